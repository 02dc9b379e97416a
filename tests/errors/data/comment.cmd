cat > j.json <<'END'
{ "recipe": "cast" } // mine
END
lemel run j.json
