"""`python -m compliance.schemas` writes the schema files."""

from compliance.schemas import write_schemas

write_schemas()
