cat > house.json <<'END'
{ "name": "Studio", "stock": {
    "Аu750 mine": { "composition": { "Au": "750 ‰", "Ag": "125 ‰", "Cu": "125 ‰" } } } }
END
lemel run jobs/links.json
