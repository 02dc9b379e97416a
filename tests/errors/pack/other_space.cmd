. "$(dirname "$0")/../make_pack.sh"
key lena trusted; sign lena file
adopt
