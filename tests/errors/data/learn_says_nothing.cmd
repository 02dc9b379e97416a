lemel learn wax_density jobs
