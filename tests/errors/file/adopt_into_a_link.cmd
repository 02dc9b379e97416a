mkdir mail
cp recipes/cast.lua mail/tin.lua
mv recipes elsewhere && ln -s elsewhere recipes
lemel adopt -q mail/tin.lua; status=$?
ls elsewhere >&2
exit $status
