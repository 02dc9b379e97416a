# Of a gauge that shows absolute pressure.
sed 's/"given"/"record": [], "given"/' jobs/links.json >jobs/g.json; lemel record jobs/g.json "gauge" "30 mbar abs"
