#compdef headhours
# Completion of headhours in zsh. Put this into a folder of $fpath, named
# _headhours, or for every new shell into ~/.zshrc, behind compinit:
#   source <(headhours completion zsh)

_headhours() {
	local line
	local -a typed names notes
	# Quotes are taken away: they are no part of a word.
	typed=("${(@)words[2,CURRENT]//[\"\'\\]/}")
	for line in "${(@f)$(headhours complete -- "${(@)typed}" 2>/dev/null)}"; do
		[[ ${typed[-1]} == --*=* ]] && compset -P '*='
		case $line in
		:files) _files; return ;;
		:folders) _files -/; return ;;
		?*)
			names+=("${line%%$'\t'*}")
			notes+=("${line/$'\t'/  }")
			;;
		esac
	done
	(( $#names )) && compadd -l -d notes -a names
}

if [[ ${funcstack[1]} == _headhours ]]; then
	_headhours "$@"
else
	compdef _headhours headhours
fi
