cat >jobs/two.json <<'J'
{ "recipe": "cast",
  "given": { "wax": "3.1 g",
             "density": "15.5 g/cm3" } }
J
for word in wish="nine" wax=3 button="9"; do lemel run jobs/two.json "$word" >/dev/null; done
