printf '{ "recipe": "account", "record": [ { "at": "2026-11-26" } ] }' >jobs/half.json && lemel book jobs/links.json jobs/half.json
