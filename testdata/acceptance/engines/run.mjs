// Runs SQL in an engine that is not the one of the tests: node run.mjs duckdb, or postgres.
// In, as JSON, are steps, one after the other: {run: statement}, {enter: schema} makes a schema and works in it,
// {load: table, file} reads a CSV file into a table, {save: table, file} writes one. Out is the engine's version.
import { readFile, writeFile } from "node:fs/promises";

const csv = "(FORMAT csv, HEADER true, NULL '\\N')";

async function duckdb() {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const connection = await (await DuckDBInstance.create(":memory:")).connect();
  const run = statement => connection.run(statement);
  return {
    run,
    enter: schema => run(`CREATE SCHEMA ${schema}; USE ${schema}`),
    load: (table, file) => run(`COPY ${table} FROM '${file}' ${csv}`),
    save: (table, file) => run(`COPY ${table} TO '${file}' ${csv}`),
    version: async () => "DuckDB " + (await connection.runAndReadAll("SELECT version()")).getRows()[0][0],
  };
}

async function postgres() {
  const { PGlite } = await import("@electric-sql/pglite");
  const database = await PGlite.create();
  const run = statement => database.exec(statement);
  await run("CREATE DOMAIN double AS double precision"); // as the others call it
  return {
    run,
    enter: schema => run(`CREATE SCHEMA ${schema}; SET search_path TO ${schema}, public`),
    load: async (table, file) =>
      database.query(`COPY ${table} FROM '/dev/blob' ${csv}`, [], { blob: new Blob([await readFile(file)]) }),
    save: async (table, file) => {
      const { blob } = await database.query(`COPY ${table} TO '/dev/blob' ${csv}`);
      await writeFile(file, Buffer.from(await blob.arrayBuffer()));
    },
    version: async () => (await database.query("SELECT version()")).rows[0].version,
  };
}

const engine = await { duckdb, postgres }[process.argv[2]]();
for (const step of JSON.parse(await new Response(process.stdin).text())) {
  try {
    if (step.run) await engine.run(step.run);
    if (step.enter) await engine.enter(step.enter);
    if (step.load) await engine.load(step.load, step.file);
    if (step.save) await engine.save(step.save, step.file);
  } catch (error) {
    console.error(`${error.message}\nin\n${JSON.stringify(step)}`);
    process.exit(1);
  }
}
console.log(await engine.version());
