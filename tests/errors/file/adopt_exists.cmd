mkdir mail; sed s/1.0.0/1.1.0/ recipes/cast.lua > mail/cast.lua; lemel adopt -q mail/cast.lua
