# A fault of the house keeps each job from being run, and is said once.
printf '{ "name": ' > house.json
lemel learn wax_density jobs
