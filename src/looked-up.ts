// Properties that are worked out each time they are asked for, of objects of which a journal has thousands.

/** What each property is made of: the same function for all objects of a kind. */
type Makers<From, Later> = { readonly [Name in keyof Later]: (from: From) => Later[Name] };

/**
 * What adds such properties to objects. A `get` written into an object is a function of its own for each, and V8 then
 * keeps all the object's properties in a form that takes some 500 bytes more; made here, they are the same for all.
 * @param how `hidden`: neither copied nor written out with the object
 * @example const withArea = lookedUp<number, { area: number }>({ area: (side) => side ** 2 });
 */
export function lookedUp<From, Later extends object>(
  makers: Makers<From, Later>,
  how: { readonly hidden?: boolean } = {},
): <Of extends object>(of: Of, from: From) => Of & Later {
  const held = Symbol('what is looked up from');
  const properties: PropertyDescriptorMap = {};
  for (const name of Object.keys(makers) as (keyof Later & string)[])
    properties[name] = {
      enumerable: !how.hidden,
      configurable: true,
      get(this: Record<typeof held, From>) {
        return makers[name](this[held]);
      },
    };
  return <Of extends object>(of: Of, from: From) => {
    Object.defineProperty(of, held, { value: from });
    return Object.defineProperties(of, properties) as Of & Later;
  };
}
