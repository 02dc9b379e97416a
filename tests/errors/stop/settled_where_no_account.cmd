# Neither its closing nor the job itself can be worked: nothing says whether it may settle.
printf '%s' '{"recipe":"cast","given":{},"record":[{"at":"2026-11-24","what":"filings","mass":"20 g","fineness":"1000 ‰","owner":"client","way":"in"}]}' >jobs/s.json; lemel record jobs/s.json "filings, settled" "0.8 g" way=settled from=filings --at 2026-12-01; grep -c settled jobs/s.json
