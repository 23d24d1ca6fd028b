#!/bin/sh
# The image lets other hosts into databases, not to replication; the nightly base backup comes from another container.
set -eu
echo "host replication $POSTGRES_USER all scram-sha-256" >> "$PGDATA/pg_hba.conf"
