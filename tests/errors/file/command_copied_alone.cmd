# The command without the scripts that come with it, gates among them: nothing is run.
mkdir -p bin share/lemel/recipes
cp "$(readlink -f "$(command -v lemel)")" bin/lemel
bin/lemel run jobs/links.json 2>&1 | sed 's, are not in [^;]*/bin/, are not in ,' >&2
bin/lemel run jobs/links.json 2>/dev/null
