"""Drawn things: tape, ruler, marks and people, as SVG text.

Imports only errors, units and its own data; geometry of people lives nowhere else.
No ``style`` attribute and no ``<style>`` element is ever written. Import the modules
themselves: people bring numpy, and tape and marks do not need it.
"""
