lemel compare pour poor jobs
