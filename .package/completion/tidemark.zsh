#compdef tidemark tidemark-viewer
# Completion for zsh: commands, options, lessons by name, else files. All asked of the program itself.

_tidemark_options() { # program and command
    "$@" --help 2>/dev/null | grep -oE -- '^  (-[a-z],)?--[a-z]+(-[a-z]+)*' | grep -oE -- '--.*'
}

_tidemark() {
    local program=$words[1] command= word=$words[CURRENT]
    if [[ ${program:t} != tidemark-viewer ]]; then
        if (( CURRENT == 2 )); then
            compadd -- ${(f)"$($program --help 2>/dev/null | awk '/^Commands:/ { on = 1; next } on && NF { print $1 }')"} --help --version
            return
        fi
        command=$words[2]
    fi
    if [[ $word == -* ]]; then
        compadd -- ${(f)"$(_tidemark_options $program $command)"}
    elif [[ $command == lesson && $words[CURRENT-1] == lesson ]]; then
        compadd -- ${(f)"$($program lesson --list 2>/dev/null | awk '{ print $2 }')"}
    else
        _files
    fi
}

_tidemark "$@"
