lemel ask gone -o jobs/new.json
