mkdir mail && cp recipes/cast.lua mail/tin.lua && lemel adopt mail/tin.lua -q --digest sha256:00; status=$?
ls recipes >&2; exit $status
