"""``cuttlebone schema``."""

import json

from cuttlebone.cli import FINE
from cuttlebone.cli.common import parser


def run(arguments: list[str]) -> int:
    """Print a JSON Schema."""
    p = parser("schema", "Print the JSON Schema of the home file (as JSON data) or of the answer.")
    p.add_argument("of", choices=("home", "answer"))
    args = p.parse_args(arguments)
    if args.of == "home":
        from cuttlebone.home.model import Household

        schema = Household.model_json_schema(by_alias=True)
    else:
        from cuttlebone.papers.document import answer_schema

        schema = answer_schema()
    print(json.dumps(schema, ensure_ascii=False, indent=2))
    return FINE
