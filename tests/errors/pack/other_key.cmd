. "$(dirname "$0")/../make_pack.sh"
key lena trusted; key stranger; sign stranger
(adopt ) 2>keys/said; status=$?; sed "s/SHA256:[^ ]*/SHA256:.../" keys/said >&2; exit $status
