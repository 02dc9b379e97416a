echo '{ "recipe": ' > jobs/links.json; lemel ask jobs/links.json given.wax
