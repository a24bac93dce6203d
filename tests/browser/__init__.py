"""Pages in a real browser. A package, so that its browser closes when its tests are over."""
