// Says what the grammars of Spark and Trino have against statements.
// In, as JSON: {name: statement}. Out, as JSON: {"Spark" or "Trino": {name: complaint, or "" when it parses}}.
import { register } from "node:module";

// dt-sql-parser is published for bundlers: its imports leave out how the names of files end.
register("data:text/javascript," + encodeURIComponent(`
  export async function resolve(name, context, next) {
    for (const end of ["", ".js", "/index.js"]) {
      try { return await next(name + end, context) } catch (error) { if (end === "/index.js") throw error }
    }
  }
`));
const { SparkSQL, TrinoSQL } = await import("dt-sql-parser");

const statements = JSON.parse(await new Response(process.stdin).text());
const complaints = {};
for (const [dialect, grammar] of [["Spark", new SparkSQL()], ["Trino", new TrinoSQL()]]) {
  complaints[dialect] = Object.fromEntries(Object.entries(statements).map(([name, statement]) =>
    [name, grammar.validate(statement).map(error => `line ${error.startLine}: ${error.message}`).join("; ")]));
}
process.stdout.write(JSON.stringify(complaints));
