cat > j.json <<'END'
{ "recipe": "pour", "date": "2026-02-30", "given": {} }
END
lemel run j.json
