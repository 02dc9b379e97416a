lemel compare cast poor jobs
