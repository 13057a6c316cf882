# Completion for bash: commands, their options, files where files are meant, lessons and words by name.
# What stands here of options is held to the programs' own --help by a test.

_tidemark_options() {
    local masses="--groups --thresholds --simplify --smallest --keep-thin --keep-light --masks --sheet-mm --crop --merge --push --name --split"
    case $1 in
    rehearse) echo "--out --threads --cell --until --frames --keep --advise --allow-outside --quiet" ;;
    look) echo "--at --out --dried --plan --allow-outside --threads" ;;
    ask) echo "--out --vary --room --paper --uncertain --whole --cell --threads --allow-outside --quiet" ;;
    check) echo "--allow-outside" ;;
    squint) echo "--out --replace $masses --paper --room --pace --start" ;;
    draft) echo "--out --replace $masses" ;;
    swatches) echo "--out --csv --paper --light" ;;
    transfer) echo "--out --grid --eye-line --head --standing $masses" ;;
    lesson) echo "--out --list --cell --threads --quiet" ;;
    viewer) echo "--size --ui-scale --cell --draft --allow-outside --script --frame-times --tell --screenshot" ;;
    esac
    echo "--help"
}

_tidemark_words() { # of an option; false: it takes none that are known
    case $1 in
    --cell) echo "0.25 0.5 1" ;;
    --light) echo "D65 D50" ;;
    --groups) echo "2 3 4 5 6 7" ;;
    --at | --until | --frames | --keep | --threads | --vary | --uncertain | --room | --paper | --thresholds | --simplify | --smallest | \
        --keep-light | --sheet-mm | --crop | --merge | --push | --name | --split | --pace | --start | --grid | --eye-line | --head | \
        --standing | --size | --ui-scale) echo ;;
    *) return 1 ;;
    esac
}

_tidemark() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]} words
    [[ ${COMP_WORDS[0]##*/} == tidemark-viewer ]] && command=viewer
    COMPREPLY=()
    compopt -o filenames 2>/dev/null
    if [[ $command != viewer && $COMP_CWORD -eq 1 ]]; then
        mapfile -t COMPREPLY < <(compgen -W "rehearse look ask check squint draft swatches transfer lesson --help --version" -- "$word")
    elif words=$(_tidemark_words "$before"); then
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
    elif [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$(_tidemark_options "$command")" -- "$word")
    elif [[ $command == lesson && $before == lesson ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$("${COMP_WORDS[0]}" lesson --list 2>/dev/null | while read -r _ name _; do echo "$name"; done)" -- "$word")
    elif [[ $before == --out && ! $command =~ ^(look|swatches|transfer)$ ]]; then
        mapfile -t COMPREPLY < <(compgen -d -- "$word")
    else
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
    fi
}

complete -F _tidemark tidemark tidemark-viewer
