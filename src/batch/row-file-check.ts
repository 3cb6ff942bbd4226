// @ts-nocheck
// Generated from row.schema.json by `npm run types`; do not edit.
// One system on a line of a JSON Lines file: where it breaks the schema.
import type { SchemaFault } from '../target/schema-fault.ts';

const validate = validate10, schema11 = { $schema: "http://json-schema.org/draft-07/schema#", $id: "tickwright.system/1", type: "object", additionalProperties: !1, properties: { name: { type: "string" }, equations: { type: "string" }, inputs: { type: "array", minItems: 1, maxItems: 20, items: { type: "string", pattern: "^[A-Za-z][A-Za-z0-9_]{0,63}$" } }, tables: { type: "object", minProperties: 1, additionalProperties: { type: "string", pattern: "^[-01]+$" } } } }, pattern0 = new RegExp("^[A-Za-z][A-Za-z0-9_]{0,63}$", "u"), pattern1 = new RegExp("^[-01]+$", "u");
function validate10(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    for (const key0 in data)
      if (!(key0 === "name" || key0 === "equations" || key0 === "inputs" || key0 === "tables")) {
        const err0 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
      }
    if (data.name !== void 0 && typeof data.name != "string") {
      const err1 = { instancePath: instancePath + "/name", schemaPath: "#/properties/name/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
    }
    if (data.equations !== void 0 && typeof data.equations != "string") {
      const err2 = { instancePath: instancePath + "/equations", schemaPath: "#/properties/equations/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
    }
    if (data.inputs !== void 0) {
      let data2 = data.inputs;
      if (Array.isArray(data2)) {
        if (data2.length > 20) {
          const err3 = { instancePath: instancePath + "/inputs", schemaPath: "#/properties/inputs/maxItems", keyword: "maxItems", params: { limit: 20 } };
          vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
        }
        if (data2.length < 1) {
          const err4 = { instancePath: instancePath + "/inputs", schemaPath: "#/properties/inputs/minItems", keyword: "minItems", params: { limit: 1 } };
          vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
        }
        const len0 = data2.length;
        for (let i0 = 0; i0 < len0; i0++) {
          let data3 = data2[i0];
          if (typeof data3 == "string") {
            if (!pattern0.test(data3)) {
              const err5 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/pattern", keyword: "pattern", params: { pattern: "^[A-Za-z][A-Za-z0-9_]{0,63}$" } };
              vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
            }
          } else {
            const err6 = { instancePath: instancePath + "/inputs/" + i0, schemaPath: "#/properties/inputs/items/type", keyword: "type", params: { type: "string" } };
            vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
          }
        }
      } else {
        const err7 = { instancePath: instancePath + "/inputs", schemaPath: "#/properties/inputs/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
      }
    }
    if (data.tables !== void 0) {
      let data4 = data.tables;
      if (data4 && typeof data4 == "object" && !Array.isArray(data4)) {
        if (Object.keys(data4).length < 1) {
          const err8 = { instancePath: instancePath + "/tables", schemaPath: "#/properties/tables/minProperties", keyword: "minProperties", params: { limit: 1 } };
          vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
        }
        for (const key1 in data4) {
          let data5 = data4[key1];
          if (typeof data5 == "string") {
            if (!pattern1.test(data5)) {
              const err9 = { instancePath: instancePath + "/tables/" + key1.replace(/~/g, "~0").replace(/\//g, "~1"), schemaPath: "#/properties/tables/additionalProperties/pattern", keyword: "pattern", params: { pattern: "^[-01]+$" } };
              vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
            }
          } else {
            const err10 = { instancePath: instancePath + "/tables/" + key1.replace(/~/g, "~0").replace(/\//g, "~1"), schemaPath: "#/properties/tables/additionalProperties/type", keyword: "type", params: { type: "string" } };
            vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
          }
        }
      } else {
        const err11 = { instancePath: instancePath + "/tables", schemaPath: "#/properties/tables/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
      }
    }
  } else {
    const err12 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
  }
  return validate10.errors = vErrors, errors === 0;
}

/** All places where the value breaks the schema; none when it keeps it. */
export function rowFaults(value: unknown): readonly SchemaFault[] {
  return validate(value) ? [] : validate.errors;
}
