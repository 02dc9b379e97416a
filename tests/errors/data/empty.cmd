cat > j.json <<'END'

END
lemel run j.json
