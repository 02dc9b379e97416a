cat > house.json <<'END'
{ "name": "Studio", "currency": "CAD",
  "units": { "mass": "g", "gewicht": "g" } }
END
lemel run cast wax='2 g' density='15 g/cm3' crucible='10 cm3' wax_density='1 g/cm3'
