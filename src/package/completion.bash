# bash completion for pullback and pullback-cli: asks the program itself, so it never goes stale
_pullback()
{
    local program=$1 word=$2 before=$3 words=
    COMPREPLY=()
    case $before in
    --lang) words='en es' ;;
    --units) words='si us' ;;
    --paper) words='a4 letter' ;;
    --grid) words='default fine' ;;
    esac
    if [ -n "$words" ]; then
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
        return
    fi
    if [ "${program##*/}" = pullback-cli ] && [ "$COMP_CWORD" -eq 1 ]; then
        words=$("$program" --help 2>/dev/null | sed -n 's/^  \([a-z]\{2,\}\) .*/\1/p')
        mapfile -t COMPREPLY < <(compgen -W "$words --help --version" -- "$word")
        return
    fi
    if [[ $word == -* ]]; then
        local verb=()
        [ "${program##*/}" = pullback-cli ] && verb=("${COMP_WORDS[1]}")
        words=$("$program" "${verb[@]}" --help 2>/dev/null | grep -o -- '--[a-z][a-z-]*' | sort -u)
        mapfile -t COMPREPLY < <(compgen -W "$words --help" -- "$word")
        return
    fi
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
    compopt -o filenames 2>/dev/null
}
complete -F _pullback pullback pullback-cli
