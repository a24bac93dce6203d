"""The pages: settings, records, services, selectors and views.

Boundary: the only package that knows Django.
Services write, selectors read; rows become core values in ``records/convert.py``, nowhere else.
"""
