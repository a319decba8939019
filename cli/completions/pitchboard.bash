# bash completion for pitchboard

_pitchboard() {
  local word=$2 before=$3 command= options= i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; ++i)); do
    case ${COMP_WORDS[i]} in
      plan | options | check | fields | packs) command=${COMP_WORDS[i]} && break ;;
    esac
  done
  case $before in
    -o | --output)
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
    '') options="plan options check fields packs --help --help-all --version" ;;
    plan) options="--output --paper --json --metric --help" ;;
    options) options="--metric --help" ;;
    check) options="--fix --metric --help" ;;
    fields) options="--schema --markdown --help" ;;
    packs) options="--help" ;;
  esac
  if [[ $command == @(plan|options|check) && $word != -* ]]; then
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -X '!*.@(toml|json)' -- "$word"; compgen -d -- "$word")
  else
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
  fi
}

complete -F _pitchboard pitchboard
