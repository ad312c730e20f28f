// Package acceptance holds the program against an independent recomputation: DuckDB reads the raw log and the tables that
// the program wrote, and the SQL of the folder sql, written from the definitions alone, must come to the same figures. An
// older DuckDB and PostgreSQL run that SQL too, and grammars of Spark and Trino parse it.
//
// It is a module of its own because the DuckDB binding needs cgo, which the program must not. Run it with
//
//	go -C testdata/acceptance test ./...
//
// The folder logs holds small shot logs with odd but valid content, reference the baseline as published (values from
// memory, as their first lines say). All players and courses are invented.
package acceptance
