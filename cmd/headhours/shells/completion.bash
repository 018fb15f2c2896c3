# Completion of headhours in bash. For every new shell, put this into ~/.bashrc:
#   source <(headhours completion bash)

_headhours() {
	local words=() word line
	# Quotes are taken away: they are no part of a word.
	for word in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
		words+=("${word//[\"\'\\]/}")
	done
	COMPREPLY=()
	while IFS= read -r line; do
		case $line in
		:files) compopt -o default ;;
		:folders) compopt -o dirnames ;;
		*)
			word=${line%%$'\t'*}
			case ${COMP_WORDS[COMP_CWORD]} in
			[\"\']*) COMPREPLY+=("$word") ;;
			*) COMPREPLY+=("$(printf %q "$word")") ;;
			esac
			;;
		esac
	done < <(headhours complete -- "${words[@]}" 2>/dev/null)
}

complete -F _headhours headhours
