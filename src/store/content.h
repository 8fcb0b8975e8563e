#pragma once

#include "changeset.h"
#include "digest.h"

// The digest of all state: a sum over the digests of every row of every state table, kept at the cost of what
// changed and recomputed by verify.
namespace ductwright::store {

RowSum recomputedSum(const Connection&, int schemaVersion);

// Takes the changes, already made in `db`, into the sum.
void takeChanges(RowSum&, const Connection& db, Bytes changeset, int schemaVersion);

RowSum storedSum(const Connection&);
void storeSum(const Connection&, const RowSum&);

}  // namespace ductwright::store
