cat > j.json <<'END'
{ "recipe": "pour", "given": { "wax": 01 } }
END
lemel run j.json
