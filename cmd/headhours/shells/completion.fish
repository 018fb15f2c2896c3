# Completion of headhours in fish. Put this into
# ~/.config/fish/completions/headhours.fish

function __headhours_complete
    set -l current (commandline -ct)
    set -l before (commandline -opc)
    # What stands before the value in --flag=value belongs to each answer.
    set -l flag (string match -r '^--[^=]+=' -- $current)
    # Quotes are taken away: they are no part of a word.
    set -l word (string replace -ra '["\'\\\\]' '' -- "$current")
    for line in (headhours complete -- $before[2..-1] $word 2>/dev/null)
        switch $line
            case :files
                __fish_complete_path $current
            case :folders
                __fish_complete_directories $current
            case '*'
                echo "$flag$line"
        end
    end
end

complete -c headhours -f -a '(__headhours_complete)'
