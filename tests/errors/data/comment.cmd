cat > j.json <<'END'
{ "recipe": "pour" } // mine
END
lemel run j.json
