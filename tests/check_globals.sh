#!/bin/sh
# The library keeps no state of its own: nothing in it can be written to. And it leaves the process alone:
# no printing, no ending, no clock, no chance, no environment, no locale. Nor does it take from the C library's
# mathematics what is not exact there: the last digit of those depends on the machine (base/real.h has our own).
# And not cJSON's parser, which writes to a global of its own.
#   check_globals.sh PATH-OF-LIBLEMEL.A
library=$1
[ -f "$library" ] || { echo "no library at $library"; exit 66; }

# Constants that hold addresses are in .data.rel.ro, which is read-only once the program is loaded.
writable=$(nm --format=sysv "$library" | awk -F'|' '
    { gsub(/[ \t]/, "", $1); gsub(/[ \t]/, "", $7) }
    $7 ~ /^(\.data|\.bss|\.tdata|\.tbss|\*COM\*)/ && $7 !~ /^\.data\.rel\.ro/ { print "    " $1 " in " $7 }')

barred='abort|atexit|clock|clock_gettime|exit|_exit|fork|fprintf|getenv|gettimeofday|gmtime|gmtime_r|localtime|localtime_r
longjmp|perror|popen|printf|cJSON_Parse|cJSON_ParseWithLength|cJSON_ParseWithLengthOpts|cJSON_ParseWithOpts
putchar|puts|raise|rand|random|setlocale|signal|sleep|srand|strerror|strtok|system|time|vfprintf|vprintf'
inexact='acos|acosh|asin|asinh|atan|atan2|atanh|cbrt|cos|cosh|erf|erfc|exp|exp10|exp2|expm1|hypot|j0|j1|jn|lgamma|log|log10|log1p|log2|pow|sin
sincos|sinh|tan|tanh|tgamma|y0|y1|yn'
called=$(nm --undefined-only --format=posix "$library" | awk -v barred="$barred|$inexact" '
    BEGIN { n = split(barred, names, /[|\n]/); for (i = 1; i <= n; i++) bad[names[i]] = 1 }
    /:$/ { file = $1; next }
    { name = $1; sub(/@.*/, "", name); sub(/^__/, "", name); sub(/_(chk|finite)$/, "", name); plain = name; sub(/[fl]$/, "", plain) }
    name in bad || plain in bad { print "    " name " in " file }')

[ -z "$writable" ] || printf 'data that can be written to:\n%s\n' "$writable"
[ -z "$called" ] || printf 'functions that are not for the library:\n%s\n' "$called"
[ "$(nm "$library" | wc -l)" -gt 100 ] || { echo "nm reads nothing from $library"; exit 70; }
[ -z "$writable$called" ]
