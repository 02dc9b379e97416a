. "$(dirname "$0")/../make_pack.sh"
key lena trusted; sign lena
lemel adopt -q mail/bench
sed -i 's/2 min/3 min/; s/10 min/15 min/; s/version = "1.0.0"/version = "1.1.0"/' mail/bench/recipes/polish.lua
lemel pack -q mail/bench version=1.1.0
rm -f mail/bench/pack.json.sig; key stranger; sign stranger
lemel adopt -q mail/bench --unsigned
