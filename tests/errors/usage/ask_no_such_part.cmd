lemel ask jobs/links.json given.wex
