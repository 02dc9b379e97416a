cp jobs/links.json fine
lemel run fine
