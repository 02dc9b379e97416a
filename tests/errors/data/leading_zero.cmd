cat > j.json <<'END'
{ "recipe": "cast", "given": { "wax": 01 } }
END
lemel run j.json
