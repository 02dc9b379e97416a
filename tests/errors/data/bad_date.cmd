cat > j.json <<'END'
{ "recipe": "cast", "date": "2026-02-30", "given": {} }
END
lemel run j.json
