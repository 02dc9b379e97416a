{ echo 'return recipe {'; head -c 300000 /dev/zero | tr '\0' ' '; echo '}'; } > recipes/big.lua
sed -i 's/"cast"/"big"/' jobs/links.json
lemel run jobs/links.json
