# Nobody writes to it: opened, it would be waited for without end.
mkfifo jobs/p.json
lemel record jobs/p.json charge mass="1 g" --at 2026-11-26
