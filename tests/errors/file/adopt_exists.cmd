mkdir mail; sed s/1.0.0/1.1.0/ recipes/pour.lua > mail/pour.lua; lemel adopt -q mail/pour.lua
