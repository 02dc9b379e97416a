cat > j.json <<'END'
{ "given": {} }
END
lemel run j.json
