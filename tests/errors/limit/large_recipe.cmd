{ echo 'return recipe {'; head -c 300000 /dev/zero | tr '\0' ' '; echo '}'; } > r.lua; lemel run r.lua
