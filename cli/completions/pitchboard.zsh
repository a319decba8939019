#compdef pitchboard

_pitchboard() {
  local -a job=('--metric[speak millimetres, whatever the job file says]' '1:job file:_files -g "*.(toml|json)"')
  local -a help=('(-h --help)'{-h,--help}'[show help]')
  local -a option=('--option[that option of the search]:number:') paper=('--paper[paper size]:paper:(letter a4)')
  local state line
  _arguments -C $help '--help-all[show the help of every command]' '--version[show the version]' '1:command:->command' '*::argument:->argument'
  case $state in
    command)
      local -a commands=(
        'plan:plan the stair and write its papers'
        'options:search all stairs, list those that nothing beats'
        'check:measure the plan against the code pack, worst first'
        'batch:plan many jobs, a line each'
        'fields:list what a job file may hold'
        'packs:list the code packs and local amendments'
        'serve:serve the page on this machine'
      )
      _describe command commands
      ;;
    argument)
      case $line[1] in
        plan)
          _arguments $help $job $option '(-o --output)'{-o,--output}'[folder for the papers]:folder:_files -/' \
            $paper '--json[print the plan as JSON]'
          ;;
        options)
          _arguments $help $job '(-o --output)'{-o,--output}'[plot of cost against comfort]:picture:_files -g "*.(svg|pdf)"' \
            $paper '(--json)--why[explain that option]:number:' '(--why)--json[print the search as JSON]'
          ;;
        batch)
          _arguments $help '1:jobs, one a line:_files' '--search[search each job and plan its pick]' '--jobs[jobs at a time]:number:'
          ;;
        check) _arguments $help $job $option '--fix[propose the least change]' ;;
        fields) _arguments $help '(--markdown)--schema[as JSON Schema]' '(--schema)--markdown[as a page]' ;;
        packs) _arguments $help ;;
        serve) _arguments $help '1:folder of the built page:_files -/' '--port[port on 127.0.0.1]:number:' ;;
      esac
      ;;
  esac
}

_pitchboard "$@"
