# The places of one C or Lua file that a mutation can change: awk -v name=engine/base/exact.c -f sites.awk FILE
# One line each: name, line, column, what stands there, what is put in its place, the line itself. What stands in comments,
# texts and directives is left alone.
BEGIN {
    lua = name ~ /\.lua$/
    # Longer ones first, so that <= is not taken for <.
    split(lua ? "<=;>=;==;~=;<;>; and ; or ;not ; + ; - ; * ; / ;true;false" \
              : "<<;>>;->;++;--;+=;-=;*=;/=;&=;|=;<=;>=;==;!=;&&;||;<;>; + ; - ; * ; / ; % ; ? ;true;false;break;", from, ";")
    split(lua ? ">;<;~=;==;<=;>=; or ; and ;; - ; + ; / ; * ;false;true" \
              : ";;;;;-=;+=;;;;;<;>;!=;==;||;&&;<=;>=; - ; + ; / ; * ; * ;;false;true;", to, ";")
    count = 0
    while (from[count + 1] != "") count++
}

function site(at, old, new) {
    printf "%s\t%d\t%d\t%s\t%s\t%s\n", name, NR, at, old, new, trimmed
}

function is_word(c) { return c ~ /[A-Za-z0-9_]/ }

{
    trimmed = $0
    gsub(/^[ \t]+|[ \t]+$/, "", trimmed)
    gsub(/\t/, " ", trimmed)
    if (!lua && /^[ \t]*#/) next
    if (!lua && !comment && /^(static )?const |^#|^}|^[a-z].*[;,]$/) next # tables and declarations outside functions
    length_of_line = length($0)
    for (at = 1; at <= length_of_line; at++) {
        c = substr($0, at, 1)
        two = substr($0, at, 2)
        if (comment) {
            if (two == "*/") { comment = 0; at++ }
            continue
        }
        if (!lua && two == "/*") { comment = 1; at++; continue }
        if (!lua && two == "//" || lua && two == "--") break
        if (c == "\"" || c == "'") {
            for (at++; at <= length_of_line && substr($0, at, 1) != c; at++)
                if (substr($0, at, 1) == "\\") at++
            continue
        }
        before = at > 1 ? substr($0, at - 1, 1) : ""
        if (c ~ /[0-9]/ && !is_word(before) && before != ".") {
            match(substr($0, at), /^[0-9][0-9A-Za-z_.]*/)
            number = substr($0, at, RLENGTH)
            if (number ~ /^[0-9]+$/ && RLENGTH < 10) site(at, number, number + 1)
            at += RLENGTH - 1
            continue
        }
        for (i = 1; i <= count; i++) {
            size = length(from[i])
            if (substr($0, at, size) != from[i]) continue
            if (from[i] ~ /^[a-z]/ && (is_word(before) || is_word(substr($0, at + size, 1)) && from[i] !~ / $/)) continue
            if (to[i] != "" || from[i] == "not " || from[i] == "break") site(at, from[i], to[i])
            at += size - (from[i] ~ /. $/ ? 2 : 1)
            break
        }
    }
}
