cat > j.json <<'END'
{ "recipe": "cast", "given": { "wax": "2 g", "density": "15 g/cm3" },
  "confirmed": { "cast/old": { "by": "O.F." } } }
END
lemel run j.json
