lemel run jobs/none.json
