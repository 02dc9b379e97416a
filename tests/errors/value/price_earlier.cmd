lemel price Au "98 USD/g" --at 2026-11-24 --from list -q; lemel price Au "99 USD/g" --at 2026-11-23 --from list
