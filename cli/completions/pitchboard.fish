# fish completion for pitchboard

set -l commands plan options check batch fields packs serve
complete -c pitchboard -f
complete -c pitchboard -s h -l help -d 'Show help'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -l help-all -d 'Show the help of every command'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -l version -d 'Show the version'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a plan -d 'Plan the stair and write its papers'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a options -d 'Search all stairs; list those that nothing beats'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a check -d 'Measure the plan against the code pack'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a batch -d 'Plan many jobs, a line each'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a fields -d 'List what a job file may hold'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a packs -d 'List the code packs and local amendments'
complete -c pitchboard -n "not __fish_seen_subcommand_from $commands" -a serve -d 'Serve the page on this machine'
complete -c pitchboard -n '__fish_seen_subcommand_from serve' -x -a '(__fish_complete_directories)'
complete -c pitchboard -n '__fish_seen_subcommand_from serve' -l port -x -d 'Port on 127.0.0.1'
complete -c pitchboard -n '__fish_seen_subcommand_from plan options check batch' -F
complete -c pitchboard -n '__fish_seen_subcommand_from plan options check' -l metric -d 'Speak millimetres'
complete -c pitchboard -n '__fish_seen_subcommand_from plan' -s o -l output -x -a '(__fish_complete_directories)' -d 'Folder for the papers'
complete -c pitchboard -n '__fish_seen_subcommand_from plan options' -l paper -x -a 'letter a4' -d 'Paper size'
complete -c pitchboard -n '__fish_seen_subcommand_from check' -l fix -d 'Propose the least change'
complete -c pitchboard -n '__fish_seen_subcommand_from plan check' -l option -x -d 'That option of the search'
complete -c pitchboard -n '__fish_seen_subcommand_from options' -s o -l output -r -F -d 'Plot of cost against comfort'
complete -c pitchboard -n '__fish_seen_subcommand_from options' -l why -x -d 'Explain that option'
complete -c pitchboard -n '__fish_seen_subcommand_from batch' -l search -d 'Search each job and plan its pick'
complete -c pitchboard -n '__fish_seen_subcommand_from batch' -l jobs -x -d 'Jobs at a time'
complete -c pitchboard -n '__fish_seen_subcommand_from plan options' -l json -d 'Print JSON'
complete -c pitchboard -n '__fish_seen_subcommand_from fields' -l schema -d 'As JSON Schema'
complete -c pitchboard -n '__fish_seen_subcommand_from fields' -l markdown -d 'As a page'
