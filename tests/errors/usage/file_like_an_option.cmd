# A file whose name begins with - is read as an option, and the command that is printed for it can be typed.
cp jobs/links.json jobs/-x.json; cd jobs
lemel run -x.json
lemel record ./-x.json tree "1 g" --at now --quiet; lemel record -q --at now -- -x.json tre "1 g"
lemel run -x
