"""The words that stand in the code to be said in other languages, found in its syntax tree."""

import ast
from pathlib import Path

import runplanner
from runplanner.scenario.starter.remarks import remarks
from runplanner.scenario.starter.starter_text import OUTFIT_TOML, YARDS_CSV
from runplanner.trade.strips import STRIPS

HOUSE = Path(runplanner.__file__).parent
SPEAKING = tuple(sorted(HOUSE.rglob("*.py")))
"""Every module of the house: what people read is said in every language."""
ONE = frozenset({"tr", "mark", "phrase"})
COUNTED = {"trn": 0, "counted": 0, "count": 1}
"""Where the sentence for one stands, the one for many behind it."""
CITED = {
    "Cited": 1, "habit": 1, "_printed": 1, "_official": 1, "_recalled": 1, "Preset": 1,
    "BookRule": 0, "SenseRule": 0,
}  # fmt: skip
"""Sources of published figures and ids of rules: text in their table, said as they are shown."""
BEYOND = 8
"""What a preset leaves to the driver stands there."""
Words = str | tuple[str, str]


def words_in_code() -> tuple[Words, ...]:
    """Every sentence and noun of the code, of the starter, and cautions of substances, once."""
    found: dict[Words, None] = {}
    for path in SPEAKING:
        found |= dict.fromkeys(words_in(path.read_text("utf-8")))
    found |= dict.fromkeys((*remarks(OUTFIT_TOML), *remarks(YARDS_CSV)))
    found |= {caution: None for known in STRIPS.values() for caution in known.cautions}
    return tuple(found)


def words_in(code: str) -> list[Words]:
    """The sentences and nouns that some code says, in order.

    What is said by a name alone (a word marked elsewhere) is not found here.
    """
    found: list[Words] = []
    for node in ast.walk(ast.parse(code)):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        name = node.func.id
        if name in ONE:
            found += _texts(node.args[:1])
        elif name in CITED:
            found += _texts(node.args[CITED[name] : CITED[name] + 1])
            found += _texts(node.args[BEYOND : BEYOND + 1]) if name == "Preset" else []
        elif name in COUNTED:
            texts = _texts(node.args[COUNTED[name] : COUNTED[name] + 2])
            found += [(texts[0], texts[1])] if len(texts) == 2 else []
    return found


def _texts(nodes: list[ast.expr]) -> list[str]:
    return [
        node.value for node in nodes if isinstance(node, ast.Constant) and type(node.value) is str
    ]


def unsayable(code: str) -> list[str]:
    """Sentences put together before they are said, and nouns without their plural.

    No catalogue can hold them.
    """
    return [ast.unparse(node) for node in ast.walk(ast.parse(code)) if _unsayable(node)]


def _unsayable(node: ast.AST) -> bool:
    if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
        return False
    name = node.func.id
    if name not in ONE and name not in COUNTED and name not in CITED:
        return False
    start = (COUNTED | CITED).get(name, 0)
    words = node.args[start : start + (2 if name in COUNTED else 1)]
    put_together = any(isinstance(arg, ast.JoinedStr | ast.BinOp) for arg in words)
    return put_together or (len(words) == 1 and name in COUNTED and bool(_texts(words)))
