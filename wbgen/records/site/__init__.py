"""A user's lawns.yaml: one file of records for each part of it, put together by `site`.

Open first: `lawn`, a record with its rules; then `site`.
"""
