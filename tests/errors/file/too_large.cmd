# The temporary file is taken away as well.
(ulimit -f 1; lemel run -q jobs/links.json --format json --sheet client -o big.json 2>&1 >/dev/null | grep -v CAUTION >&2)
ls -A | grep big >&2
exit 74
