# The folder of the studio is there, and nobody may look into it: the usual settings do not take its place.
mkdir -p away/jobs && cp jobs/links.json away/jobs && ln -s loop away/house.json && ln -s house.json away/loop
lemel run away/jobs/links.json
