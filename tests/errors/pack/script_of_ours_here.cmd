. "$(dirname "$0")/../make_pack.sh"
mkdir scripts && echo "return {}" > scripts/taxes.lua
lemel run -q cast wax="1 g" density="7 g/cm3"
