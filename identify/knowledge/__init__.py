"""YAML tables and rules in, validated frozen values out; every fault with its file and line.

`yaml_reader` reads YAML strictly and keeps line numbers, `fields` checks one mapping field by
field and collects faults, the other modules build the catalogue and the rule book. Nothing else
in the package opens a data file.
"""
