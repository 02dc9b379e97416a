lemel compare pour jobs
