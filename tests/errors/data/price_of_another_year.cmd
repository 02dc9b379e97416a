export LEMEL_NOW=2099-12-31T12:00
lemel price Au "98.50 USD/g" --at 2026-11-24 --from r -q
lemel price Au "98.60 USD/g" --at 2099-11-25 --from r
