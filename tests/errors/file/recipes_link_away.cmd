rm -r recipes
ln -s /nowhere recipes
lemel run jobs/links.json
