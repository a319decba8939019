#compdef pitchboard

_pitchboard() {
  local -a job=('--metric[speak millimetres, whatever the job file says]' '1:job file:_files -g "*.(toml|json)"')
  local -a help=('(-h --help)'{-h,--help}'[show help]')
  local state line
  _arguments -C $help '--help-all[show the help of every command]' '--version[show the version]' '1:command:->command' '*::argument:->argument'
  case $state in
    command)
      local -a commands=(
        'plan:plan the stair and write its papers'
        'options:list the flights that fit, best first'
        'check:measure the plan against the code pack, worst first'
        'fields:list what a job file may hold'
        'packs:list the code packs and local amendments'
      )
      _describe command commands
      ;;
    argument)
      case $line[1] in
        plan)
          _arguments $help $job '(-o --output)'{-o,--output}'[folder for the papers]:folder:_files -/' \
            '--paper[paper size]:paper:(letter a4)' '--json[print the plan as JSON]'
          ;;
        options) _arguments $help $job ;;
        check) _arguments $help $job '--fix[propose the least change]' ;;
        fields) _arguments $help '(--markdown)--schema[as JSON Schema]' '(--schema)--markdown[as a page]' ;;
        packs) _arguments $help ;;
      esac
      ;;
  esac
}

_pitchboard "$@"
