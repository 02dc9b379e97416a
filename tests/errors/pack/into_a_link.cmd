. "$(dirname "$0")/../make_pack.sh"
mv recipes mail/recipes && ln -s mail/recipes recipes; before=$(state)
adopt --unsigned
