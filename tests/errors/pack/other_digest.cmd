. "$(dirname "$0")/../make_pack.sh"
(adopt --digest sha256:0000000000000000000000000000000000000000000000000000000000000000) 2>keys/said; status=$?; sed "s/it is sha256:[0-9a-f]*/it is sha256:.../" keys/said >&2; exit $status
