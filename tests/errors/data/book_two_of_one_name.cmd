mkdir old && sed 's/2 g/3 g/' jobs/links.json >old/links.json && lemel book jobs/links.json old/links.json
