# Completion for fish: the viewer's options, held to its own --help by a test.

complete -c tidemark-viewer -s h -l help -d 'what it can do'
complete -c tidemark-viewer -l size -x
complete -c tidemark-viewer -l ui-scale -x
complete -c tidemark-viewer -l cell -x
complete -c tidemark-viewer -l draft
complete -c tidemark-viewer -l allow-outside
complete -c tidemark-viewer -l script -r
complete -c tidemark-viewer -l frame-times
complete -c tidemark-viewer -l tell
complete -c tidemark-viewer -l screenshot -r
