lemel compare cast jobs
