# bash completion for pitchboard

_pitchboard() {
  local word=$2 before=$3 command= options= i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; ++i)); do
    case ${COMP_WORDS[i]} in
      plan | options | check | batch | fields | packs | serve) command=${COMP_WORDS[i]} && break ;;
    esac
  done
  case $before in
    -o | --output)
      if [[ $command == options ]]; then
        compopt -o filenames 2>/dev/null
        mapfile -t COMPREPLY < <(compgen -f -X '!*.@(svg|pdf)' -- "$word"; compgen -d -- "$word")
        return
      fi
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$word")
      return
      ;;
    --paper)
      mapfile -t COMPREPLY < <(compgen -W "letter a4" -- "$word")
      return
      ;;
  esac
  case $command in
    '') options="plan options check batch fields packs serve --help --help-all --version" ;;
    plan) options="--option --output --paper --json --metric --help" ;;
    options) options="--why --output --paper --json --metric --help" ;;
    check) options="--option --fix --metric --help" ;;
    batch) options="--search --jobs --help" ;;
    fields) options="--schema --markdown --help" ;;
    packs) options="--help" ;;
    serve) options="--port --help" ;;
  esac
  if [[ $command == @(plan|options|check) && $word != -* ]]; then
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -X '!*.@(toml|json)' -- "$word"; compgen -d -- "$word")
  elif [[ $command == serve && $word != -* ]]; then
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -d -- "$word")
  elif [[ $command == batch && $word != -* ]]; then
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
  else
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
  fi
}

complete -F _pitchboard pitchboard
