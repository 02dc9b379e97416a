lemel ask jobs/links.json given..wax
