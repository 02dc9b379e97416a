. "$(dirname "$0")/../make_pack.sh"
key lena trusted; sign lena; mkdir keys/bin; ln -s "$(command -v lemel)" keys/bin/lemel
lemel=$(command -v lemel); PATH=keys/bin:$PWD/keys/bin "$lemel" adopt -q mail/bench
