"""What the YAML files say: frozen records, checked in themselves and against each other.

In: trees of `wbgen.files.yaml` and a `Report`. Out: the catalogue (`catalogue`) and the site (`site.site`). A record
and its rules stand in one file; whoever holds a record may rely on it.

Open `product` for the catalogue and `site.site` for a user's lawns.yaml; `fields` has the values that both are made
of.
"""
