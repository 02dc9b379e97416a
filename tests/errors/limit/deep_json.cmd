{ printf '{ "recipe": "cast", "given": '; head -c 100 /dev/zero | tr '\0' '['; echo; } > j.json; lemel run j.json
