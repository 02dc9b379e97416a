sed -i 's/"cast"/"gone"/' jobs/links.json; lemel ask jobs/links.json given.wax
