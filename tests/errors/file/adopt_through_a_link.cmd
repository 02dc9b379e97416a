mkdir mail elsewhere
sed 's/1.0.0/1.1.0/' recipes/cast.lua > mail/cast.lua
mv recipes/cast.lua elsewhere/cast.lua && ln -s ../elsewhere/cast.lua recipes/cast.lua
lemel adopt -q mail/cast.lua --replace; status=$?
grep -c 1.1.0 elsewhere/cast.lua >&2
exit $status
