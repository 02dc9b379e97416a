# What it withholds is what it fails with: check says no more of it than run does.
printf '%s' '{"recipe":"wire","given":{"thickness":"20 mm","ring_inside":"100 mm","metal":"Ag925 sterling"},"house":{"ring_most":"10 g"}}' >jobs/w.json; lemel check jobs/w.json
