cat > jobs/jar.json <<'EOF'
{ "recipe": "topup", "given": { "melt": "31.2 g", "melt_fineness": "752 ‰", "needed": "34 g", "promised": "750 ‰", "jars": [
  { "name": "grain", "fineness": "755 ‰" } ] },
  "record": [ { "at": "2026-11-26T14:30", "what": "added garin", "mass": "1.4 g" } ],
  "house": { "scale_step": "0.01 g" } }
EOF
lemel run jobs/jar.json
