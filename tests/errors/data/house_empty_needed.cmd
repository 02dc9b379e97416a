# Of the recipes with such a setting some do without it: the one that needs it says so.
mkdir new && cd new && lemel new studio name=Loft place=US currency=USD mass=g -q && lemel check house.json 2>&1 | grep -A1 "scale_step" >&2; exit 65
