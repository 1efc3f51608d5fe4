"""The demo site with salty water, a leachate to aim at, and beans in its soil."""

import shutil
from pathlib import Path

from scheduler.files.demo import demo_source


def salty_site(folder: Path) -> Path:
    """Copy the demo site and enter 900 uS/cm of water, 5 mS/cm of leachate."""
    shutil.copytree(demo_source() / "tern_hollow", folder)
    salt = {
        "site.toml": [("[supply]", "water_ec_us_per_cm = 900")],
        "zones.toml": [
            ("[zone.pots]", "leachate_ec_ms_per_cm = 5.0"),
            ("[zone.soil]", 'salt_crop = "bean"'),
        ],
    }
    for name, lines in salt.items():
        text = (folder / name).read_text("utf-8")
        for table, line in lines:
            assert f"{table}\n" in text
            text = text.replace(f"{table}\n", f"{table}\n{line}\n")
        (folder / name).write_text(text, encoding="utf-8")
    return folder
