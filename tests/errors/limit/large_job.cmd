{ echo '{'; head -c 5000000 /dev/zero | tr '\0' ' '; echo '}'; } > j.json; lemel run j.json
