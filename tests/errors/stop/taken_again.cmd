# More goes back into the crucible than the button weighed, and more is handed back than is left of it, in a job with no account yet.
printf '%s' '{"recipe":"account","record":[{"at":"2026-11-27T15:00","what":"button","mass":"16.37 g"}]}' >jobs/s.json
take() { lemel record -q jobs/s.json "$@" owner=client fineness="585 ‰" --at 2026-11-28; }
take "weighed button" "20 g" way=melted from=button
take "weighed button" "14.31 g" way=melted from=button
take "button, handed back" "3.06 g" way=returned from=button
take "button, handed back" "2.09 g" way=returned from=button
take "button, handed back" "2.08 g" way=returned from=button
take "button, sent" "1 g" way=sent from=button
grep -c '"from":"button"' jobs/s.json
take "button, sent" "1 g" way=sent from=button --anyway
