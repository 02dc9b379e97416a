# A weighing that no box has, typed again, would count twice in the metal account.
lemel record -q jobs/links.json "spare bit" "1 g" way=here owner=client fineness="585 ‰" --at 2026-12-01T09:00
lemel record jobs/links.json "spare bit" "1.1 g" way=here owner=client fineness="585 ‰" --at 2026-12-01T10:00
for way in returned kept sent; do
    lemel record -q jobs/links.json "$way bit" "1 g" way=$way owner=client fineness="585 ‰" --at 2026-12-01T11:00
    lemel record jobs/links.json "$way bit" "1 g" way=$way owner=client fineness="585 ‰" --at 2026-12-01T12:00
done
