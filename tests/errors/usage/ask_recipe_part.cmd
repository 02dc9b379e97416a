lemel ask cast wax -o jobs/other.json
