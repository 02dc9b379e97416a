printf '{"lemel":"0.2.0","results":{}}' >jobs/need.json && lemel book jobs
