"""How is a page opened in a browser, and what is it heard to say?"""

import re
import subprocess


def opened(browser, page, profile, *options, size=(900, 700)):
    """The page's elements after its scripts have run, and what it said on its console."""
    done = subprocess.run(
        ["timeout", "-k", "5", "90", browser, "--headless", "--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
         f"--user-data-dir={profile}", f"--window-size={size[0]},{size[1]}", "--virtual-time-budget=8000", "--enable-logging=stderr",
         "--host-resolver-rules=MAP * ~NOTFOUND", *options, "--dump-dom", page.as_uri()],
        capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout, re.findall(r"^.*CONSOLE.*$", done.stderr, re.MULTILINE)
