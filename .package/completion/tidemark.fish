# Completion for fish: commands and their options.
# What stands here of options is held to the programs' own --help by a test.

complete -c tidemark -n __fish_use_subcommand -f -a rehearse -d 'paint a plan and write what comes of it'
complete -c tidemark -n __fish_use_subcommand -f -a look -d 'the sheet at any moment of a kept rehearsal'
complete -c tidemark -n __fish_use_subcommand -f -a ask -d 'what if: variants side by side'
complete -c tidemark -n __fish_use_subcommand -f -a check -d 'read a plan and all it names'
complete -c tidemark -n __fish_use_subcommand -f -a squint -d 'the few value masses of a picture'
complete -c tidemark -n __fish_use_subcommand -f -a draft -d 'a first plan from a photograph'
complete -c tidemark -n __fish_use_subcommand -f -a swatches -d 'a chart of every pigment'
complete -c tidemark -n __fish_use_subcommand -f -a transfer -d 'what is traced onto the paper'
complete -c tidemark -n __fish_use_subcommand -f -a lesson -d 'one effect of water on paper'
complete -c tidemark -n __fish_use_subcommand -l version -d 'the version'
complete -c tidemark -s h -l help -d 'what it can do'
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l threads -x
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l cell -x
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l until -x
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l frames -x
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l keep -x
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l advise
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l allow-outside
complete -c tidemark -n '__fish_seen_subcommand_from rehearse' -l quiet
complete -c tidemark -n '__fish_seen_subcommand_from look' -l at -x
complete -c tidemark -n '__fish_seen_subcommand_from look' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from look' -l dried
complete -c tidemark -n '__fish_seen_subcommand_from look' -l plan -r
complete -c tidemark -n '__fish_seen_subcommand_from look' -l allow-outside
complete -c tidemark -n '__fish_seen_subcommand_from look' -l threads -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l vary -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l room -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l paper -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l uncertain
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l whole
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l cell -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l threads -x
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l allow-outside
complete -c tidemark -n '__fish_seen_subcommand_from ask' -l quiet
complete -c tidemark -n '__fish_seen_subcommand_from check' -l allow-outside
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l replace
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l groups -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l thresholds -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l simplify -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l smallest -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l keep-thin
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l keep-light -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l masks -r
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l sheet-mm -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l crop -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l merge -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l push -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l name -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l split -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l paper -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l room -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l pace -x
complete -c tidemark -n '__fish_seen_subcommand_from squint' -l start -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l replace
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l groups -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l thresholds -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l simplify -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l smallest -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l keep-thin
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l keep-light -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l masks -r
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l sheet-mm -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l crop -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l merge -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l push -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l name -x
complete -c tidemark -n '__fish_seen_subcommand_from draft' -l split -x
complete -c tidemark -n '__fish_seen_subcommand_from swatches' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from swatches' -l csv -r
complete -c tidemark -n '__fish_seen_subcommand_from swatches' -l paper -x
complete -c tidemark -n '__fish_seen_subcommand_from swatches' -l light -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l grid -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l eye-line -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l head -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l standing -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l groups -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l thresholds -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l simplify -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l smallest -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l keep-thin
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l keep-light -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l masks -r
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l sheet-mm -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l crop -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l merge -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l push -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l name -x
complete -c tidemark -n '__fish_seen_subcommand_from transfer' -l split -x
complete -c tidemark -n '__fish_seen_subcommand_from lesson' -l out -r
complete -c tidemark -n '__fish_seen_subcommand_from lesson' -l list
complete -c tidemark -n '__fish_seen_subcommand_from lesson' -l cell -x
complete -c tidemark -n '__fish_seen_subcommand_from lesson' -l threads -x
complete -c tidemark -n '__fish_seen_subcommand_from lesson' -l quiet
