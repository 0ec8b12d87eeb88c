"""Checks the log of an unpacked archive with nothing of Layerbook: python3 rehash.py FOLDER. Prints the number of entries.

Each line's body is hashed in a form made here, by the standard library (RFC 8785 for text and whole numbers: keys in order of
UTF-16 units, no white space, characters as they are), compared with the text as it stands and with `hash`, and the chain walked.
"""
import hashlib, json, pathlib, sys


def canonical(value):
    if isinstance(value, dict):
        keys = sorted(value, key=lambda key: key.encode("utf-16-be"))
        return "{" + ",".join(canonical(key) + ":" + canonical(value[key]) for key in keys) + "}"
    if isinstance(value, list):
        return "[" + ",".join(canonical(item) for item in value) + "]"
    assert not isinstance(value, float), f"{value}: no fraction is ever hashed"
    return json.dumps(value, ensure_ascii=False)


count = 0
for log in sorted(pathlib.Path(sys.argv[1], "data/log").glob("*.jsonl")):
    before = None
    for line in log.read_text(encoding="utf-8").splitlines():
        entry = json.loads(line)
        body = canonical(entry["body"])
        assert line.startswith('{"body":' + body + ',"hash":'), f"{log.name}: body is not in its canonical form"
        assert hashlib.sha256(body.encode()).hexdigest() == entry["hash"], f"{log.name}: hash differs"
        assert entry["body"]["prev"] == before, f"{log.name}: chain broken"
        before = entry["hash"]
        count += 1
print(count)
